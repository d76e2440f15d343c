import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { buildHull } from '@ribband/hull';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import { forgetRead } from '../repair.loaders.js';
import { SurveyType, ScopeType } from '../survey/survey.types.js';
import { tellConditions, tellScope } from '../survey/tell-scope.js';
import { tellPreview } from './tell-preview.js';
import type { WorkChange } from './work-change.js';
import { Work } from './work.service.js';
import { MethodsType, WorkChangeInput, WorkPayload, WorkPreviewType } from './work.types.js';

const PreviewWorkResult = refusable('PreviewWorkResult', () => WorkPreviewType);
const ApplyWorkResult = refusable('ApplyWorkResult', () => WorkPayload);

@Resolver()
export class WorkResolver {
  constructor(@Inject(Work) private readonly work: Work) {}

  @AllowSignedIn()
  @Query(() => SurveyType, {
    nullable: true,
    description: 'What was found on the hull; null before a survey.',
  })
  async survey(@CurrentCaller() caller: Caller): Promise<SurveyType | null> {
    const { hull, survey } = await this.work.records(caller);
    if (!hull || !survey) return null;
    return { ...survey, conditions: tellConditions(buildHull(hull.outline), survey.survey).slice(0, 2000) };
  }

  @AllowSignedIn()
  @Query(() => ScopeType, {
    nullable: true,
    description: 'What is to be opened and done; null before a survey.',
  })
  async scope(@CurrentCaller() caller: Caller): Promise<ScopeType | null> {
    const { hull } = await this.work.records(caller);
    const found = await this.work.scope(caller);
    return hull && found && tellScope(buildHull(hull.outline), found);
  }

  @AllowSignedIn()
  @Query(() => MethodsType, {
    nullable: true,
    description: 'How work is done here; null before a book is kept.',
  })
  async methods(@CurrentCaller() caller: Caller): Promise<MethodsType | null> {
    return (await this.work.records(caller)).methods;
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => PreviewWorkResult, {
    description: 'What a change of outline, survey or methods would do to the tasks; nothing is done.',
  })
  async previewWork(
    @CurrentCaller() caller: Caller,
    @Args('change', { type: () => WorkChangeInput, description: 'What is to change.' })
    change: WorkChangeInput,
  ): Promise<WorkPreviewType> {
    const preview = await this.work.preview(caller, changeOf(change));
    return Object.assign(new WorkPreviewType(), tellPreview(preview));
  }

  @Allow('director', 'shipwright')
  @Mutation(() => ApplyWorkResult, {
    description: 'Changes outline, survey or methods, and whatever follows from them of the tasks, at once.',
  })
  async applyWork(
    @CurrentCaller() caller: Caller,
    @Args('change', { type: () => WorkChangeInput, description: 'What is to change.' })
    change: WorkChangeInput,
    @Context() context: RequestContext,
  ): Promise<WorkPayload> {
    forgetRead(context);
    const { hull, survey, methods } = await this.work.apply(caller, changeOf(change));
    return Object.assign(new WorkPayload(), {
      outlineVersion: hull?.version ?? null,
      surveyVersion: survey?.version ?? null,
      methodsVersion: methods?.version ?? null,
    });
  }
}

function changeOf(input: WorkChangeInput): WorkChange {
  const { outlineVersion = null, surveyVersion = null, methodsVersion = null, reason = null } = input;
  const given = (value: unknown): boolean => value !== undefined && value !== null;
  return {
    ...(given(input.outline) ? { outline: { value: input.outline, version: outlineVersion } } : {}),
    ...(given(input.survey) ? { survey: { value: input.survey, version: surveyVersion } } : {}),
    ...(given(input.methods) ? { methods: { value: input.methods, version: methodsVersion } } : {}),
    reason,
  };
}
